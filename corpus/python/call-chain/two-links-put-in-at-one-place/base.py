qs = q.filter(s).order_by("time")
