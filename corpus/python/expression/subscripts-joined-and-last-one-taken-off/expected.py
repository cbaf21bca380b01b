def weight(graph, i, j):
<<<<<<< ours
    return graph.edge[i][j].get(KEY, 1)
=======
    return graph.edge[i, j][KEY]
>>>>>>> theirs
