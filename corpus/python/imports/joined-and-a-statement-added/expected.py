from tideboard.model import High, Low, Spring

KINDS = [High, Low, Spring]
