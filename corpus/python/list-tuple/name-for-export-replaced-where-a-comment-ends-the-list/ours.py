__all__ = [
    'charts', 'feeds', 'ports', 'api', 'stats',
    'station',
    'gauge',  # deprecated, use 'station' instead
]

charts = load('charts')
