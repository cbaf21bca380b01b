<<<<<<< ours
import harbour.feeds
=======
import tideboard.sources
>>>>>>> theirs
