from tideboard.model import High
from tideboard.model import Low
from tideboard.model import Spring

KINDS = [High, Low, Spring]
