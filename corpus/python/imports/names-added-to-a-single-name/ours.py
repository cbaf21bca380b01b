from tideboard import feeds, ports

feeds.start()
