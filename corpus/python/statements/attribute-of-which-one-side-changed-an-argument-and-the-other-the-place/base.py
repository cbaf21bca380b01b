def setup(self, folder, **options):
    os.makedirs(folder)
    self.board = Board(folder)
    feeds = Feeds.from_url("tides.sqlite", folder)
    create(feeds)
    self.board.start()
