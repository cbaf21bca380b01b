def f(a):
  if a:
    # note
    x(a)
  return a
