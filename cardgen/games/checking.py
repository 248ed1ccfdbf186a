"""A quick check: what is asked in every row, what there is to choose from, and where the right answer stands."""

import random
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cardgen.errors import TeacherError
from cardgen.games.checking_choices import Bar, FoilKeys, bar_as_foil, worth_of
from cardgen.games.checking_marks import chance, checked_mark
from cardgen.games.checking_signs import SignName, signs_for
from cardgen.games.checking_words import ByKey, Picker, Stock
from cardgen.games.naming import this_is
from cardgen.games.orders import even_order, orders_without_runs
from cardgen.games.pieces import CheckPart, CheckTask, CheckVersion, Choice
from cardgen.request import CheckRequest, PartKind
from cardgen.words.contrast import By, Contrast
from cardgen.words.pool import PoolWord
from cardgen.words.sounds import Sound

# With two choices five right of five would be needed, and no slip allowed: eight allow one.
DEFAULT_ITEMS = {2: 8, 3: 5}
LONGEST_RUN = 2


@dataclass(frozen=True, slots=True)
class Checked:
    """The parts of a check in every version, the words in them, and what the teacher should know of both."""

    versions: tuple[CheckVersion, ...]
    words: tuple[PoolWord, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CheckGame:
    """What a check is made of: the lesson's sounds, the older ones, their words, what is mixed up, the row signs."""

    lesson: tuple[Sound, ...]
    review: tuple[Sound, ...]
    stock: Stock
    close: tuple[Contrast, ...]
    signs: tuple[SignName, ...]

    @property
    def sounds(self) -> tuple[Sound, ...]:
        """All sounds, the lesson's first."""
        return self.lesson + self.review


def check(request: CheckRequest, game: CheckGame, rng: random.Random) -> Checked:
    """Return the parts that are asked for; TeacherError where sounds, words or items do not make a check."""
    plans = [_plan(request, game, kind) for kind in request.wanted_parts]
    signs = signs_for([plan.items for plan in plans], game.signs, game.lesson, game.review)
    maker = _Maker(game, rng, Picker(game.stock, rng, set()), rng.sample(game.lesson, len(game.lesson)))
    parts = tuple(maker.part(number, plan, own) for number, (plan, own) in enumerate(zip(plans, signs, strict=True)))
    names = request.versions or ("",)
    versions = [CheckVersion(names[0], parts)]
    versions += [CheckVersion(name, tuple(_shifted(part, rng) for part in parts)) for name in names[1:]]
    notes = (*_fresh(maker, game), *_apart(parts, game), *_tested(parts, game), *maker.notes)
    return Checked(tuple(versions), tuple(maker.words.values()), notes)


@dataclass(frozen=True, slots=True)
class _Plan:
    kind: PartKind
    foils: FoilKeys
    choices: int
    items: int
    older: tuple[Sound, ...]


def _plan(request: CheckRequest, game: CheckGame, kind: PartKind) -> _Plan:
    """Settle how many choices and rows a part has; TeacherError where there is nothing to choose between."""
    beside = [sound for sound in game.sounds if not kind.rings_pictures or game.stock.shown[sound.key]]
    foils = FoilKeys(beside, not kind.rings_pictures, worth_of(game.close, by_letter=not kind.rings_pictures))
    able = game.stock.said if kind is PartKind.HEAR_LETTER else game.stock.shown
    choices = foils.choices(game.lesson)
    older = _older(game, foils, able, choices)
    if len(game.lesson) == 1 and not older and choices > 2:
        choices, older = 2, _older(game, foils, able, 2)
    if choices < 2 or (len(game.lesson) == 1 and not older):
        raise _no_choice(game, foils, kind)
    items = DEFAULT_ITEMS[choices] if request.items is None else request.items
    checked_mark(items, choices)
    return _Plan(kind, foils, choices, items, older)


def _older(game: CheckGame, foils: FoilKeys, able: ByKey, choices: int) -> tuple[Sound, ...]:
    """Return the older sounds that can be asked too: those with words and with enough wrong choices."""
    return tuple(sound for sound in game.review if able[sound.key] and foils.sets(sound, choices - 1))


def _no_choice(game: CheckGame, foils: FoilKeys, kind: PartKind) -> TeacherError:
    """Return the error that names a sound beside which nothing wrong can stand, and why."""
    if len(game.lesson) == 1 and foils.sets(game.lesson[0], 1):
        return TeacherError(
            f"In the part {kind.value} every answer would be {game.lesson[0].key}: no other sound can be asked there.",
            "Name another sound that was taught, for example --review m",
        )
    alone = next(sound for sound in game.lesson if not foils.sets(sound, 1))
    bars = [
        f"{sound.key} ({found.value})"
        for sound in game.sounds
        if sound is not alone and (found := bar_as_foil(sound, alone, by_letter=foils.by_letter))
    ]
    because = f": not {', '.join(bars)}" if bars else ""
    return TeacherError(
        f"In the part {kind.value} there is no wrong choice for {alone.key}{because}.",
        "Name another sound that was taught, for example --review m",
    )


@dataclass
class _Maker:
    """Makes one part after the other, and keeps what was used."""

    game: CheckGame
    rng: random.Random
    picker: Picker
    order: list[Sound]

    def __post_init__(self) -> None:
        self.words: dict[str, PoolWord] = {}
        self.asked: dict[str, set[str]] = {}
        self.notes: list[str] = []

    def part(self, number: int, plan: _Plan, signs: Sequence[str]) -> CheckPart:
        wanted = self._shares(number, plan)
        keys = list(wanted)
        asked = [keys[kind] for kind in orders_without_runs(list(wanted.values()), LONGEST_RUN, self.rng)]
        places = even_order(plan.items, plan.choices, LONGEST_RUN, self.rng)
        rows = self._rows(plan, wanted, asked)
        tasks = tuple(
            self._task(plan.kind, sign, key, row, place)
            for sign, key, row, place in zip(signs, asked, rows, places, strict=True)
        )
        mark = checked_mark(plan.items, plan.choices)
        return CheckPart(number + 1, plan.kind, tasks, plan.choices, mark, chance(plan.items, plan.choices, mark))

    def _shares(self, number: int, plan: _Plan) -> dict[str, int]:
        """Return how often each sound is asked: the lesson's evenly; an older one once, so that it is no idle choice.

        One sound alone would always be the answer: then half of the rows ask older ones.
        """
        lesson, older, items = self.order, plan.older, plan.items
        room_for_older = bool(older) and items > 2 * len(lesson)
        back = items // 2 if len(lesson) == 1 else int(room_for_older)
        shares = _dealt(items - back, [sound.key for sound in lesson], number)
        return shares | _dealt(back, [sound.key for sound in older], number)

    def _rows(self, plan: _Plan, wanted: dict[str, int], asked: Sequence[str]) -> list["_Row"]:
        """Choose the words of a part: what is said, what is seen, and what there is to choose from."""
        kind, name, taken = plan.kind, plan.kind.value, set[str]()
        seen = self.picker.take(wanted, taken, seen=True, part=name) if kind is not PartKind.HEAR_LETTER else None
        said = self.picker.take(wanted, taken, seen=False, part=name) if kind.names_a_word else None
        for words in (seen, said):
            for key, entries in (words or {}).items():
                self._keep(entries)
                self.asked.setdefault(key, set()).update(entry.word.word for entry in entries)
        shown = Counter(taken)
        by_key = {sound.key: sound for sound in self.game.sounds}
        rows = []
        for key in asked:
            own = _Row(seen[key].pop() if seen else None, said[key].pop() if said else None, [])
            for foil in plan.foils.pick(by_key[key], plan.choices - 1, self.rng):
                own.foils.append(Choice(foil, foil) if not kind.rings_pictures else self._foil(foil, own, shown, name))
            rows.append(own)
        if kind.rings_pictures:
            self._note_repeats(rows, shown, name)
        return rows

    def _foil(self, key: str, row: "_Row", shown: Counter[str], part: str) -> Choice:
        entry = self.picker.foil(key, row.pictures, shown, part)
        row.pictures.append(entry.word)
        self._keep([entry])
        return Choice(entry.word.word, key, entry.word.picture)

    def _keep(self, entries: Iterable[PoolWord]) -> None:
        for entry in entries:
            self.words.setdefault(entry.word.word, entry)

    def _note_repeats(self, rows: Sequence["_Row"], shown: Counter[str], part: str) -> None:
        often = sorted(word for word, count in shown.items() if count > 1)
        if often:
            self.notes.append(
                f"In {part} these stand in more than one row, as no more go together: {', '.join(often)}."
            )

    def _task(self, kind: PartKind, sign: str, key: str, row: "_Row", place: int) -> CheckTask:
        sound = next(sound for sound in self.game.sounds if sound.key == key)
        foils = row.foils
        self.rng.shuffle(foils)
        if kind.rings_pictures and row.seen:
            right = Choice(row.seen.word.word, key, row.seen.word.picture)
        else:
            right = Choice(key, key)
        choices = [*foils[:place], right, *foils[place:]]
        if not kind.rings_pictures:
            choices = [self._letter(kind, choice.key) for choice in choices]
        heard = row.said or (row.seen if kind.is_seen else None)
        return CheckTask(
            sign,
            key,
            heard.word.word if heard else sound.say,
            this_is(row.seen.word) if row.seen and kind.is_seen else "",
            row.seen.word.picture if row.seen and kind.is_seen else None,
            tuple(choices),
            place,
        )

    def _letter(self, kind: PartKind, key: str) -> Choice:
        sound = next(sound for sound in self.game.sounds if sound.key == key)
        return Choice(sound.capital if kind is PartKind.SEE_CAPITAL else sound.letter, key)


class _Row:
    """The words of one row: the picture asked about or right, the word said, the wrong choices."""

    def __init__(self, seen: PoolWord | None, said: PoolWord | None, foils: list[Choice]) -> None:
        self.seen, self.said, self.foils = seen, said, foils
        self.pictures = [seen.word] if seen else []


def _dealt(count: int, keys: Sequence[str], turn: int) -> dict[str, int]:
    """Return `count` things dealt evenly to the keys; who gets one more moves on with every turn."""
    if not keys or count == 0:
        return {}
    share, more = divmod(count, len(keys))
    first = turn * more % len(keys)
    return {key: share + ((place - first) % len(keys) < more) for place, key in enumerate(keys)}


def _shifted(part: CheckPart, rng: random.Random) -> CheckPart:
    """Return the part with the right answer of every row in another place, as evenly and with as short runs as before.

    All places move on by the same step, so what is true of the one order is true of the other.
    """
    step = rng.randrange(1, part.choices)
    tasks = []
    for task in part.tasks:
        place = (task.place + step) % part.choices
        foils = [choice for choice in task.choices if choice is not task.answer]
        rng.shuffle(foils)
        tasks.append(replace(task, choices=(*foils[:place], task.answer, *foils[place:]), place=place))
    return replace(part, tasks=tuple(tasks))


def _fresh(maker: _Maker, game: CheckGame) -> list[str]:
    """Say for every sound how many of its words the lesson's bingo does not use."""
    counts = {key: (len(words - game.stock.lesson), len(words)) for key, words in maker.asked.items() if words}
    listed = ", ".join(f"{key} {new} of {all_}" for key, (new, all_) in counts.items())
    lines = [f"Words asked that the bingo of these sounds and this seed does not use: {listed}."]
    few = [key for key, (new, all_) in counts.items() if new < min(2, all_)]
    if few:
        lines.append(f"For {' and '.join(few)} there are no more fresh words.")
    return lines


def _apart(parts: Sequence[CheckPart], game: CheckGame) -> list[str]:
    """Say which sounds never stand in one row, and why."""
    by_letter = any(not part.kind.rings_pictures for part in parts)
    told: set[frozenset[str]] = set()
    lines: dict[Bar, list[str]] = {}
    spelled: list[str] = []
    for asked in game.sounds:
        for foil in game.sounds:
            pair = frozenset([asked.key, foil.key])
            found = bar_as_foil(foil, asked, by_letter=by_letter) if foil is not asked else None
            if found is Bar.SPELLING:
                spelled.append(f"{foil.key} for {asked.key}")
            elif found and pair not in told:
                told.add(pair)
                lines.setdefault(found, []).append(f"{asked.key} – {foil.key}")
    said = [f"Never in one row: {', '.join(pairs)} ({found.value})." for found, pairs in lines.items()]
    if spelled:
        said.append(f"Never a wrong letter: {', '.join(spelled)} ({Bar.SPELLING.value}).")
    return said


def _tested(parts: Sequence[CheckPart], game: CheckGame) -> list[str]:
    """Say which hard pairs stand in one row, so that they are really told apart."""
    rows = {frozenset([task.key, choice.key]) for part in parts for task in part.tasks for choice in task.choices}
    reasons = {By.HOME: "hard for these learners", By.EAR: "close by ear", By.EYE: "alike to the eye"}
    found: dict[str, str] = {}
    for by, why in reasons.items():
        for contrast in game.close:
            if contrast.by is by and len(contrast.keys) == 2 and frozenset(contrast.keys) in rows:
                found.setdefault(" – ".join(contrast.keys), why)
    if not found:
        return []
    return ["Hard pairs stand side by side on purpose: " + ", ".join(f"{p} ({why})" for p, why in found.items()) + "."]
