from tideboard import feeds, charts, alerts

feeds.start()
