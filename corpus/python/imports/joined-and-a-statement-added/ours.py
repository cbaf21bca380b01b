from tideboard.model import High, Low

KINDS = [High, Low]
