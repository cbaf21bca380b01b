class A:
    def f(self):
        return 1

    def g(self):
        return 2
