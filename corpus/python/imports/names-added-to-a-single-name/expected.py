from tideboard import feeds, ports, alerts

feeds.start()
