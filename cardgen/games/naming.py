"""How a picture is named in a sentence: "This is a mouse.", "This is soup.", "These are grapes."."""

from cardgen.words.bank import Word
from cardgen.words.sounds import is_vowel

# Words that take no article in the singular, and those that are more than one; all others are counted things.
_UNCOUNTED = frozenset([
    "autumn", "bread", "celery", "chalk", "cheese", "chess", "chocolate", "corn", "earth", "eight", "eleven",
    "fire", "five", "four", "glue", "ham", "honey", "ice", "ice-cream", "ink", "jam", "jelly", "juice",
    "ketchup", "milk", "nine", "oatmeal", "off", "oil", "on", "one", "open", "ouch", "out", "paint", "popcorn",
    "quiet", "rain", "salt", "seven", "shampoo", "six", "soap", "soup", "string", "ten", "thirteen", "thread",
    "three", "two", "under", "underwear", "up", "upside-down", "water", "yarn", "yogurt", "zero",
])  # fmt: skip
_PLURAL = frozenset([
    "antlers", "dice", "earmuffs", "earphones", "gloves", "goggles", "grapes", "instruments", "jeans",
    "noodles", "numbers", "overalls", "pants", "peas", "scissors", "shorts", "sunglasses", "vegetables",
])  # fmt: skip


def this_is(word: Word) -> str:
    """Return the sentence that names a picture. "a" or "an" goes by the first sound: a unicorn, an apple."""
    name = word.word
    if name in _PLURAL:
        return f"These are {name}."
    if name in _UNCOUNTED or (word.group == "number" and name.isalpha()):
        return f"This is {name}."
    return f"This is {'an' if is_vowel(word.phones[0]) else 'a'} {name}."
