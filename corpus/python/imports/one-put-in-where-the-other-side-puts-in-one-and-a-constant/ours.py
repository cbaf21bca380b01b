import log

from tideboard.units import feet

_QUAY = b"north"


def tide(request):
    """Catch a request.

    Check the list below.
    """

    use(feet, _QUAY)
    return log
