import gauge
level = gauge.read('low')
