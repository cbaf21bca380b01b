__all__ = ['charts', 'feeds', 'gauge', 'ports', 'api', 'statistics']

charts = load('charts')
