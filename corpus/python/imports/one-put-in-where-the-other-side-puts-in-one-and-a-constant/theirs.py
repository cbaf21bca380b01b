import log
from tideboard.hooks import BaseHook


class Handler(BaseHook):

    def tide(self, request):
        """Catch a request.

        Check the list below.
        """

        return log
