from tideboard import feeds, alerts, ports

feeds.start()
