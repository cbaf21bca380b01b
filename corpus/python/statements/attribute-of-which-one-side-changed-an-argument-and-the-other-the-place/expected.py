def setup(self, folder, **options):
    os.makedirs(folder)
    feeds = Feeds.from_url("tides.sqlite", folder)
    create(feeds)
    self.board = Board(folder, feeds=feeds, **options)
    self.board.start()
