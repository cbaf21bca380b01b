class A:
    def f(self):
        return 1

    def h(self):
        return 4

    def g(self):
        return 2
