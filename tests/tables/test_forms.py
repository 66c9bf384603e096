"""Forms of DATA give back their bytes and stand in any BASIC's quotes."""

import random

import pytest

from scenekit.errors import EncodingError
from scenekit.tables.forms import (
    SIGNS,
    from_decimal,
    from_hexadecimal,
    from_radix,
    to_decimal,
    to_hexadecimal,
    to_radix,
)


def test_radix_by_hand():
    # 0x00 0x10 0x83 = 000000 000001 000010 000011; signs 0 to 3
    assert to_radix(bytes([0x00, 0x10, 0x83])) == "0123"
    # one byte 255 = 111111 11(0000): signs 63 and 48
    assert to_radix(b"\xff") == SIGNS[63] + SIGNS[48] == "pa"


def test_hexadecimal_and_decimal_by_hand():
    assert to_hexadecimal(b"\x0f\xa0") == "0FA0"
    assert to_decimal(b"\x01\x02\x03") == (258, 768)


def test_signs_need_no_escape():
    assert len(SIGNS) == len(set(SIGNS)) == 64
    assert not set(SIGNS) & set("\"'\\, &#$%{}~\n")
    assert all(48 <= ord(sign) <= 112 for sign in SIGNS)


@pytest.mark.parametrize("length", range(12))
def test_bytes_come_back(length):
    for seed in range(20):
        data = random.Random(100 * length + seed).randbytes(length)
        assert from_radix(to_radix(data)) == data
        assert from_hexadecimal(to_hexadecimal(data)) == data
        assert from_decimal(to_decimal(data))[:length] == data


def test_wrong_signs_are_refused():
    with pytest.raises(EncodingError, match="radix"):
        from_radix("01\\")
    with pytest.raises(EncodingError, match="hexadecimal"):
        from_hexadecimal("0G")
    with pytest.raises(EncodingError, match="0 to 65535"):
        from_decimal((65_536,))
