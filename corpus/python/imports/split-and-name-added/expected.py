from tideboard.model import High
from tideboard.model import Low, Neap, Spring

KINDS = [High, Low, Neap]
