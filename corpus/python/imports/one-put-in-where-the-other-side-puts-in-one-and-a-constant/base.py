import log


def tide(request):
    """Catch a request.

    Check the list below.
    """

    return log
