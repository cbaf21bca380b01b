class FeedTest(Case):
    def test_rows(self):
        self.read_rows()

    def close(self):
        yield self.close_the_feed()
        yield self.close_the_reactor()
