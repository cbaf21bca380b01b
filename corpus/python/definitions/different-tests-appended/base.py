import pytest

from tideboard.units import metres


def test_feet():
    assert metres(10, "ft") == 3.048
