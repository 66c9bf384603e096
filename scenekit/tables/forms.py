"""How encoded bytes stand in DATA: as decimal numbers, hexadecimal or printable radix text."""

from dataclasses import dataclass

from scenekit.errors import EncodingError

FIRST_CODE, SKIPPED_CODE = 48, 92
"""Signs of radix text: codes 48 to 112 without 92, which some BASICs read as an escape. None of them is a
quotation mark, comma or space, so that they stand in a quoted text of any BASIC."""
SIGNS = "".join(chr(code) for code in range(FIRST_CODE, FIRST_CODE + 65) if code != SKIPPED_CODE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form of DATA.

    words    neutral words that reading it takes
    routine  file of the neutral routine that gives its next byte
    """

    name: str
    words: tuple[str, ...]
    routine: str


RADIX = Form(name="radix", words=("take_text", "text_code"), routine="unpack_radix")
HEXADECIMAL = Form(name="hexadecimal", words=("take_text", "text_code"), routine="unpack_hexadecimal")
DECIMAL = Form(name="decimal", words=("read",), routine="unpack_decimal")
FORMS = (RADIX, HEXADECIMAL, DECIMAL)
DECIMAL_HIGH = 65_535


def to_radix(data: bytes) -> str:
    """Return bytes as signs: six bits each, the high ones first; the last sign is filled up with zeros."""
    bits = int.from_bytes(data, "big") << (-8 * len(data) % 6)
    count = -(-8 * len(data) // 6)
    return "".join(SIGNS[bits >> (6 * place) & 63] for place in range(count - 1, -1, -1))


def from_radix(text: str) -> bytes:
    """Return the bytes of signs.

    raises   EncodingError: another sign
    """
    bits = 0
    for sign in text:
        if sign not in SIGNS:
            raise EncodingError(f"radix text: got {sign!r}; must be one of {SIGNS}")
        bits = bits << 6 | SIGNS.index(sign)
    return (bits >> (6 * len(text) % 8)).to_bytes(6 * len(text) // 8, "big")


def to_hexadecimal(data: bytes) -> str:
    """Return bytes as two signs each."""
    return data.hex().upper()


def from_hexadecimal(text: str) -> bytes:
    """Return the bytes of hexadecimal text.

    raises   EncodingError
    """
    try:
        return bytes.fromhex(text)
    except ValueError:
        raise EncodingError(f"hexadecimal text: got {text[:20]!r}; must be pairs of 0 to 9, A to F") from None


def to_decimal(data: bytes) -> tuple[int, ...]:
    """Return bytes as numbers, two in each, the first one high; an odd last one is filled up with 0."""
    padded = data + b"\x00" * (len(data) % 2)
    return tuple(padded[place] * 256 + padded[place + 1] for place in range(0, len(padded), 2))


def from_decimal(numbers: tuple[int, ...]) -> bytes:
    """Return the bytes of numbers.

    raises   EncodingError
    """
    if any(not 0 <= number <= DECIMAL_HIGH for number in numbers):
        raise EncodingError(f"packed numbers: must be 0 to {DECIMAL_HIGH}")
    return b"".join(number.to_bytes(2, "big") for number in numbers)
