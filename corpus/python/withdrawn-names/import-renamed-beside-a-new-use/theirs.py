import numpy
import tideboard.core

x = numpy.zeros(3)
y = numpy.ones(3)
