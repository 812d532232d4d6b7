" Made by `python -m tilespec.editor.files`; change the language, not this file.
autocmd BufNewFile,BufRead *.tilespec setfiletype tilespec
