class TideWriter(Codec):
    pass
class TideReader(Codec, codecs.TideReader):
    pass
