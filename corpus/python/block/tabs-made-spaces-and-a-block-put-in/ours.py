class A:
    def f(self, a):
        if a:
            x(1)
        return 1

    def g(self):
        return 2
