class FeedTest(TestCase):
    def setUp(self):
        self.master = fake_master()

    def feed(self, harbour, user):
        return Feed(harbour, user)

    def test_added(self):
        feed = self.feed("north", "warden")
        feed.read(self.event)
        self.assertEqual(len(self.master.tides_added), 1)
        tide = self.master.tides_added[0]
        self.assertEqual(tide["harbour"], "north")
