import numpy
import tideboard.core

x = numpy.zeros(3)
