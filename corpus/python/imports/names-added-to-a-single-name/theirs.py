from tideboard import feeds, alerts

feeds.start()
