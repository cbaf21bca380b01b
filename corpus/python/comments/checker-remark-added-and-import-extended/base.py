from tideboard import feeds
from tideboard import model
