import numpy as np
import tideboard.core

x = np.zeros(3)
<<<<<<< ours
=======
y = numpy.ones(3)
>>>>>>> theirs
