<<<<<<< ours
import tideboard.predict as predict
=======
import tideboard.predict as forecast
>>>>>>> theirs
import tideboard.units as units
