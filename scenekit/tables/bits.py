"""Numbers in as few bits as the largest needs: nibbles, single bits and what lies between."""

from collections.abc import Sequence

from scenekit.errors import EncodingError
from scenekit.tables.encoding import Bytes, Encoding

MOST_BITS = 7


def encode(numbers: Sequence[int], wide: int, row: int) -> bytes | None:
    """Return the number of bits, then all numbers, the first in the lowest bits; None from 8 bits on."""
    bits = max((number.bit_length() for number in numbers), default=1) or 1
    if bits > MOST_BITS:
        return None
    packed = sum(number << (bits * place) for place, number in enumerate(numbers))
    return bytes([bits]) + packed.to_bytes((bits * len(numbers) + 7) // 8, "little")


def decode(data: Bytes, count: int, wide: int) -> list[int]:
    """Return the numbers."""
    bits = data.byte()
    if not 1 <= bits <= MOST_BITS:
        raise EncodingError(f"bits: got {bits} bits a number; must be 1 to {MOST_BITS}")
    held, kept, numbers = 0, 0, []
    for _ in range(count):
        if held < bits:
            kept += data.byte() << held
            held += 8
        numbers.append(kept % (1 << bits))
        kept >>= bits
        held -= bits
    return numbers


PLUGIN = Encoding(
    name="bits",
    code=1,
    meaning="as few bits a number as the largest needs",
    encode=encode,
    decode=decode,
    routine="unpack_bits",
    example=((1, 2, 15, 0, 9), 1, 0, bytes([4, 0x21, 0x0F, 0x09])),
)
