from tideboard.model import High, Low, Neap

KINDS = [High, Low, Neap]
