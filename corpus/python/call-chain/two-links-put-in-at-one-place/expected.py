<<<<<<< ours
qs = q.filter(s).exclude(bad=1).order_by("time")
=======
qs = q.filter(s).distinct().order_by("time")
>>>>>>> theirs
