__all__ = [
    'charts', 'feeds', 'ports', 'api', 'statistics',
    'station',
    'gauge',  # deprecated, use 'station' instead
]

charts = load('charts')
