package main

// floors are the packages from the top of the house to the bottom. An import leads from a
// floor to one below it, never up and never along; a package that is on no floor, or a floor
// without one, fails the test.
var floors = [][]string{
	{"cmd/dryfit"},
	{"cmd/dryfit/live", "cmd/dryfit/world", "cmd/dryfit/photos", "cmd/dryfit/notices", "cmd/dryfit/house"},
	{"cmd/dryfit/disk", "cmd/dryfit/stdout"},
	{"render/live"},
	{"render/pack", "render/quote", "render/survey"},
	{"render/pack/planfile"},
	{"render/book", "render/drawing", "render/order"},
	{"render/table/heating", "render/curves"},
	{"render/table"},
	{"render/table/lists"},
	{"render/schematic", "render/isometric", "render/detail", "render/template", "render/sticker", "render/cutplan", "render/year"},
	{"render/schematic/arrange", "render/isometric/picture"},
	{"render/isometric/members"},
	{"render/tag"},
	{"render/sheet", "render/symbol", "render/label", "render/isometric/space", "render/schematic/place"},
	{"render/scene", "render/photo", "render/schematic/engine"},
	{"render/schematic/layoutcache", "render/table/form"},
	{"graph/whatif", "graph/match"},
	{"graph/plan"},
	{"graph/plan/search"},
	{"graph/plan/advice"},
	{"graph/plan/stage", "graph/retrofit/removal"},
	{"graph/retrofit", "graph/takeoff", "graph/rule", "graph/practice"},
	{"graph/retrofit/draft", "graph/retrofit/lead", "graph/route/solid", "graph/hydraulic/spread", "graph/heat/job", "graph/takeoff/stock"},
	{"graph/hydraulic"},
	{"graph/route/laying"},
	{"graph/route", "graph/description"},
	{"graph/description/pipework"},
	{"graph/description/field"},
	{"graph/settle"},
	{"graph/stream", "graph/description/located", "graph/description/schema", "graph/description/meaning", "graph/description/layout", "graph/hydraulic/laws", "graph/heat", "graph/sample"},
	{"graph", "graph/hydraulic/network"},
	{"catalog/tables", "graph/hydraulic/formula"},
	{"catalog"},
	{"catalog/data"},
	{"catalog/quantity"},
}

// forTests are packages that only tests import.
var forTests = []string{"graph/agree", "graph/golden", "graph/lots", "graph/patch", "graph/said", "render/scene/differ", "graph/description/ladder", "graph/hydraulic/twin"}
