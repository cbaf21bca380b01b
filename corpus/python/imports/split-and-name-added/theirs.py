from tideboard.model import High, Low, Neap, Spring

KINDS = [High, Low, Neap]
