class FeedTest(Case):
    def test_rows(self):
        self.read_rows()

    def close(self):
        return self.close_the_feed()
