from tideboard import feeds, charts, alerts, ports

feeds.start()
