import subprocess
import sys

from cardgen.sources import dictionary


def test_every_reading_in_order() -> None:
    assert dictionary.readings("umbrella")[0][:2] == ("AH0", "M")
    assert dictionary.readings("umbrella")[1][:2] == ("AH1", "M")
    assert dictionary.readings("Moon") == (("M", "UW1", "N"),)


def test_an_unknown_word_has_no_reading() -> None:
    assert dictionary.readings("blorf") == ()
    assert dictionary.readings("ice cream") == ()


def test_comments_in_the_dictionary_are_stripped() -> None:
    import pronouncing

    pronouncing.init_cmu()
    commented = [word for word, text in pronouncing.pronunciations if "#" in text]
    assert commented, "the dictionary no longer has entries with a comment: the stripping can go"
    for word in commented:
        for phones in dictionary.readings(word):
            assert phones
            assert all(phone.rstrip("012").isalpha() and phone.isupper() for phone in phones)


def test_the_dictionary_is_loaded_only_for_a_word_outside_the_bank() -> None:
    code = (
        "import sys\nfrom cardgen import ask\n"
        "ask.sounds(); ask.words(('m', 's')); ask.word(['moon', 'fox', 'umbrella'], None)\n"
        "assert 'pronouncing' not in sys.modules\n"
        "ask.word(['gorilla'], 'g')\n"
        "assert 'pronouncing' in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
