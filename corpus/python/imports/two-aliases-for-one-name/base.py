import tideboard.predict
import tideboard.units
