import numpy as np
import tideboard.core

x = np.zeros(3)
