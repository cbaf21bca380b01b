def f(a):
	for b in a:
		x(b)
	return a
