def weight(graph, i, j):
    return graph.edge[i, j].get(KEY, 1)
