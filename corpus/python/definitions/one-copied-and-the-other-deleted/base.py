class TideWriter(Codec, codecs.TideWriter):
    pass
class TideReader(Codec, codecs.TideReader):
    pass
