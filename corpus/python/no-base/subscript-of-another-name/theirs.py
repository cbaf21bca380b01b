low = 1

Rows = Level[gauge.Row[Port], Port]
