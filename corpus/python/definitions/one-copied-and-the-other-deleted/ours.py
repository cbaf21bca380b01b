class TideReader(Codec, codecs.TideReader):
    if buffered:
        pass
class TideReader(Codec, codecs.SurgeReader):
    pass
