"""Text to syntax tree; the only importer of Lark and of pint."""
