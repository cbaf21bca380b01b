import harbour.feeds
