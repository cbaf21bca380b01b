import tideboard.predict as predict
import tideboard.units
