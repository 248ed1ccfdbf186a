"""Addresses behind the codes: which may be printed, how the address of a recording is made, how it is shown.

An address is checked as it was written and never changed: only its scheme and host are blind to case (RFC 3986, 6.2.2),
and a code must lead where she meant.
"""

import re
from collections.abc import Sequence

from cardgen.errors import TeacherError

LONGEST = 200  # letters; a code for more has modules too fine for a phone
LEAST_MODULE = 0.5  # mm
INDEX = "index"
SUFFIX = ".html"
EXAMPLE = "https://clips.example.org/year1"

# The letters an address is made of (RFC 3986, 2); others are written with a per cent sign.
_LETTERS = re.compile(r"[A-Za-z0-9\-._~:/?#\[\]@!$&'()*+,;=%]*")
_PARTS = re.compile(r"([A-Za-z][A-Za-z0-9+.\-]*):(.*)", re.DOTALL)
_HOST = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9.\-]*[A-Za-z0-9])?(:\d{1,5})?")
_PAGE = re.compile(r"\.(html?|php|aspx?|m4a|mp3|ogg|wav)$", re.IGNORECASE)


def check_address(address: str, where: str = "") -> str:
    """Return the address as it was written, if it may stand behind a code; TeacherError saying what is wrong.

    `where` is told first: the line of a list, for example.
    """
    lead = f"{where}: " if where else ""
    shown = address if len(address) <= 60 else f"{address[:60]} …"
    if len(address) > LONGEST:
        raise TeacherError(
            f"{lead}the link {shown} has {len(address)} letters.",
            f"At most {LONGEST}: longer ones make codes too fine for a phone. Shorten the names of its folders.",
        )
    if re.search(r"\s", address):
        raise TeacherError(f'{lead}there is a space in the link "{shown}".', "Copy it from the line of the browser.")
    parts = _PARTS.fullmatch(address)
    scheme = parts[1].lower() if parts else ""
    if parts is None or scheme not in ("https", "http") or not parts[2].startswith("//"):
        raise TeacherError(f'{lead}"{shown}" is no link to a page.', f"Links begin with https://, like {EXAMPLE}")
    if not _LETTERS.fullmatch(address):
        wrong = next(letter for letter in address if not _LETTERS.fullmatch(letter))
        raise TeacherError(f'{lead}the link {shown} has a "{wrong}" in it.', "Copy it from the line of the browser.")
    host = re.split(r"[/?#]", parts[2][2:], maxsplit=1)[0]
    if "@" in host:
        raise TeacherError(
            f"{lead}The link names a user or a password before its @.",
            "Whoever has the code could read it: put the recordings where no password is asked, "
            "or give families the password on paper.",
        )
    if not _HOST.fullmatch(host):
        raise TeacherError(f'{lead}"{shown}" leads to no site.', f"Write it like {EXAMPLE}")
    return address


def check_folder(link: str) -> str:
    """Return the link to the folder of the listening pages, if names can be put after it; TeacherError if not."""
    check_address(link)
    if "?" in link or "#" in link:
        raise TeacherError(
            "The link has a ? or # in it, so no name of a recording can follow it.",
            "Give the folder in which the pages lie, or every recording's own link with --links FILE.csv.",
        )
    if _PAGE.search(link.split("//", 1)[1].partition("/")[2]):
        raise TeacherError(
            "The link leads to a single page or file, not to the folder in which the pages lie.",
            "Leave out what follows the last / .",
        )
    return link


def address_of(link: str, name: str) -> str:
    """Return the address of a recording's page: the folder's link, the name, `.html`; TeacherError if too long."""
    return check_address(f"{link.rstrip('/')}/{name}{SUFFIX}")


def shown(address: str) -> str:
    """Return an address as it is printed to be typed: without its scheme."""
    return address.split("//", 1)[1]


def warnings(addresses: Sequence[str]) -> tuple[str, ...]:
    """Return what to look out for in some addresses, each thing once."""
    lines = []
    open_ones = [address for address in addresses if address.lower().startswith("http:")]
    if open_ones:
        lines.append(
            f"The link {shown(open_ones[0])} is not protected (http): phones may warn, and others can read along. "
            "Use https if your site has it."
        )
    asking = [address for address in addresses if "?" in address]
    if asking:
        lines.append(
            f"The link {shown(asking[0])} has a ? in it: what follows often tells who shared it. No name of a child or "
            "a family may stand there."
        )
    return tuple(lines)


def too_fine(address: str, module: float) -> str:
    """Return the warning for a code whose modules are `module` mm wide; empty where a phone reads it easily."""
    if module >= LEAST_MODULE - 1e-9:
        return ""
    return (
        f"The link {shown(address)} has {len(address)} letters, so its code is fine: {module:.2f} mm a square, where "
        f"phones like {LEAST_MODULE:g}. A shorter link is read more surely."
    )
