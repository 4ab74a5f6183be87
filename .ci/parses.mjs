// Parses a text with a grammar of tree-sitter and fails where it does not parse:
// node parses.mjs GRAMMAR.wasm FILE, from a folder in which web-tree-sitter is installed.
import { readFileSync } from "node:fs";
import { Language, Parser } from "web-tree-sitter";

await Parser.init();
const parser = new Parser();
parser.setLanguage(await Language.load(process.argv[2]));
let wrong = 0;
const look = (node) => {
	if (node.isError || node.isMissing) {
		wrong++;
		console.log(`${process.argv[3]}:${node.startPosition.row + 1}:${node.startPosition.column + 1}: does not parse`);
	}
	for (let i = 0; i < node.childCount; i++) { look(node.child(i)); }
};
look(parser.parse(readFileSync(process.argv[3], "utf8")).rootNode);
process.exit(wrong > 0 ? 1 : 0);
