class A:
	def f(self, a):
		if a:
			x(1, 2)
			if b:
				y()
		return 1

	def g(self):
		return 3

	def h(self):
		for a in b:
			return a
