class FeedTest(Case):
    def test_rows(self):
        self.read_rows()

    def close(self):
<<<<<<< ours
=======
        yield self.close_the_feed()
>>>>>>> theirs
        yield self.close_the_reactor()
