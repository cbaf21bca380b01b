class FeedTest(TestCase):
    def setUp(self):
        self.master = fake_master()

    def feed(self, harbour, user, **options):
        return Feed(harbour, user, **options)

    def test_added(self):
        feed = self.feed("north", "warden")
        feed.read(self.event)
        self.assertEqual(len(self.master.updates.tidesAdded), 1)
        tide = self.master.updates.tidesAdded[0]
        self.assertEqual(tide["harbour"], "north")
