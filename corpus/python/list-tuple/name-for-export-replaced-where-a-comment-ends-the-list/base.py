__all__ = ['charts', 'feeds', 'gauge', 'ports', 'api', 'stats']

charts = load('charts')
