from tideboard.model import High
from tideboard.model import Low, Neap

KINDS = [High, Low, Neap]
