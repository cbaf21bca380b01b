from tideboard import feeds, charts

feeds.start()
