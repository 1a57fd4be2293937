module haywarden

go 1.26.0
