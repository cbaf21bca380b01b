def f(a):
  if a:
    x(a)
  return a
