import tideboard.predict as forecast
import tideboard.units as units
