import pytest

from tideboard.units import metres


def test_feet():
    assert metres(10, "ft") == 3.048


def test_unknown_unit():
    with pytest.raises(KeyError):
        metres(1, "cubit")


@pytest.mark.parametrize("height", [0, 1.5])
def test_metres(height):
    assert metres(height, "m") == height
