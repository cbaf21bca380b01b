<<<<<<< ours
tides = load(path=self.workdir, unit='m')
=======
tides = load(path=path, unit='m')
>>>>>>> theirs
