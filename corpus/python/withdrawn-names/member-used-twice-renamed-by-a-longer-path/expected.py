class FeedTest(TestCase):
    def setUp(self):
        self.master = fake_master()

<<<<<<< ours
    def feed(self, harbour, user, **options):
        return Feed(harbour, user, **options)
=======
    def feed(self, harbour, user, *gauges):
        return Feed(harbour, user, *gauges)
>>>>>>> theirs

    def test_added(self):
        feed = self.feed("north", "warden")
        feed.read(self.event)
        self.assertEqual(len(self.master.updates.tidesAdded), 1)
        tide = self.master.updates.tidesAdded[0]
        self.assertEqual(tide["harbour"], "north")

    def test_merged(self):
        feed = self.feed("south", "warden")
        feed.read(self.merged_event)
        self.assertEqual(len(self.master.tides_added), 1)
        self.assertEqual(self.master.tides_added[0]["harbour"], "south")
