<<<<<<< ours
=======
class TideWriter(Codec):
    pass
>>>>>>> theirs
class TideReader(Codec, codecs.TideReader):
    if buffered:
        pass
class TideReader(Codec, codecs.SurgeReader):
    pass
