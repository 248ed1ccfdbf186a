"""What the teacher's page says of paper and hands: how to print, how to cut, about how long it takes."""

from cardgen.games.pieces import Cut, PaperUse

CARE = (
    "A grown-up cuts with blades and laminates; round the corners afterwards.",
    "Your school's own rules and local law come first.",
)


def count(number: int, noun: str) -> str:
    """Return a number with its noun, in the plural where it must be: "1 cut", "12 cuts"."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def in_short(use: PaperUse) -> str:
    """Return paper, cuts and minutes in a few words, for the line that a teacher reads first."""
    if use.by_hand and use.scissors:
        cuts = f"{count(use.scissors, 'cut')} with scissors"
    else:
        cuts = f"{count(use.cuts, 'cut')}, about {count(use.minutes, 'minute')}" if use.cuts else "no cuts"
    return f"{count(use.sheets, 'sheet')}, {cuts}"


def sheets_line(use: PaperUse) -> str:
    """Return how many sheets of what, and about how much ink they take."""
    (what, first), *others = use.parts
    listed = ", ".join([f"{count(first, 'sheet')} of {what}", *(f"{number} of {what}" for what, number in others)])
    return f"{listed}; about {max(1, round(use.ink * 100))} % of the paper is inked (an estimate)."


def cuts_line(use: PaperUse, cut: Cut) -> str:
    """Return how many cuts there are and about how long they take; the minutes are a rule of thumb."""
    if not use.scissors:
        return "Nothing to cut."
    if cut is Cut.SCISSORS:
        return f"{count(use.scissors, 'cut')} with scissors along the thin lines."
    return (
        f"{count(use.cuts, 'guillotine cut')} in stacks of ten, about {count(use.minutes, 'minute')} "
        f"(a rule of thumb), or {use.scissors} cuts with scissors."
    )


def cards_lines(use: PaperUse, cut: Cut, *, sets: int = 1, whole: str = "set") -> tuple[str, ...]:
    """Return what there is to know of printing and cutting loose cards; `whole` is what one pile makes up."""
    lines = [f"{sheets_line(use)} {cuts_line(use, cut)}"]
    if cut is Cut.GUILLOTINE and use.cuts:
        lines.append(
            "Keep the sheets in order. Make all upright cuts, lay the strips together again, then make the level cuts."
        )
    if sets > 1:
        piles = (
            f"Each pile, or a few piles side by side, is one {whole}, in order; the small number on a card is its "
            f"{whole}."
        )
        mixed = (
            f"Cut, and lay the piles onto one another: the {whole}s come in order; the small number on a card is its "
            f"{whole}."
        )
        lines.append(mixed if use.mixed_piles else piles)
    lines.append(printing_line(use))
    if use.marks_at_edge:
        lines.append(
            "The marks at top and bottom lie so near to the edge that this printer may leave them out: set the back "
            "stop of the guillotine, or choose smaller cards."
        )
    return tuple(lines)


def printing_line(use: PaperUse) -> str:
    """Return how to print: at true size, on which sides."""
    if use.folded:
        sides = "on one side. Fold each sheet along its middle, glue it, then cut: the backs meet the fronts"
    elif use.turned_on:
        sides = (
            f"on both sides, turned on the {use.turned_on} edge (`cardgen ruler` shows how well yours meets); an empty "
            "page keeps backs behind their fronts"
        )
    else:
        sides = "on one side"
    return f"Print at 100 %, {sides}. The bar below is 100 mm long."
