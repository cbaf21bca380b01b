import log
from tideboard.hooks import BaseHook

from tideboard.units import feet

_QUAY = b"north"


class Handler(BaseHook):

    def tide(self, request):
        """Catch a request.

        Check the list below.
        """

        use(feet, _QUAY)
        return log
