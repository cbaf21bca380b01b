import os
<<<<<<< ours
from quay.net import Request, Reply
=======
from quay.net import Reply, HarbourRequest as Request
>>>>>>> theirs
