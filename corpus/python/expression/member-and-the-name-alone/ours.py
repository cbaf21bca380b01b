tides = load(path=self.workdir, unit='m')
