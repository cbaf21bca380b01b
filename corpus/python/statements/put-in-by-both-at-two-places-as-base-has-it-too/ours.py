def test_gauge(client):
    answer = client.get("/tide")
    assert answer.status == 200
    assert "high" in answer.text

    client.debug = True
    with raises(KeyError) as error:
        client.get("/tide")

    assert "low" in str(error)
    answer = client.get("/alarm")
    assert answer.status == 200

    client.debug = False
    client.config["STRICT"] = True
    with raises(KeyError):
        client.get("/tide")
