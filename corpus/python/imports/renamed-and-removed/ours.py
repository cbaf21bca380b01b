from tideboard import charts as plots, feeds

feeds.start()
