class FeedTest(TestCase):
    def setUp(self):
        self.master = fake_master()

    def feed(self, harbour, user, *gauges):
        return Feed(harbour, user, *gauges)

    def test_added(self):
        feed = self.feed("north", "warden")
        feed.read(self.event)
        self.assertEqual(len(self.master.tides_added), 1)
        tide = self.master.tides_added[0]
        self.assertEqual(tide["harbour"], "north")

    def test_merged(self):
        feed = self.feed("south", "warden")
        feed.read(self.merged_event)
        self.assertEqual(len(self.master.tides_added), 1)
        self.assertEqual(self.master.tides_added[0]["harbour"], "south")
