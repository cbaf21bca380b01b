def test_gauge(client):
    answer = client.get("/gauge")
    assert answer.status == 200
    assert "high" in answer.text

    client.config["STRICT"] = True
    with raises(KeyError) as error:
        client.get("/gauge")

    assert "low" in str(error)
