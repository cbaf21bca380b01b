from tideboard import feeds, charts, ports

feeds.start()
