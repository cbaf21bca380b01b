__all__ = [
    'charts', 'feeds', 'ports', 'api',
    'station',
    'gauge',  # deprecated, use 'station' instead
    'statistics',
]

charts = load('charts')
