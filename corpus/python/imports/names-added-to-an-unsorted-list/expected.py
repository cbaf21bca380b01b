from tideboard import feeds, charts, ports, alerts

feeds.start()
