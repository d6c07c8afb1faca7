autocmd BufNewFile,BufRead *.finw setfiletype finwright
