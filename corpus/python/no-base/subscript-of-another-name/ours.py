low = 1

Rows = Level[Either[Port, gauge.Row[Port]], Port]
