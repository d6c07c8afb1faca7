;;; finwright-mode.el --- Edit hobby-rocket descriptions  -*- lexical-binding: t; -*-

;; Package-Requires: ((emacs "28.1"))

;;; Commentary:

;; A mode for *.finw files: comments, indentation, colours, and the finwright language server through Eglot.
;; The colours go by shape alone: what a word means is the server's business, so no list of words can go stale here.

;;; Code:

(defgroup finwright nil
  "Edit hobby-rocket descriptions."
  :group 'languages)

(defcustom finwright-command '("finwright" "lsp")
  "The command that starts the language server."
  :type '(repeat string))

(defcustom finwright-indent 2
  "How far a block's lines stand in from the block."
  :type 'natnum)

(defvar finwright-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?_ "_" table)
    table))

(defvar finwright-font-lock-keywords
  '(("^\\s-*\\(let\\|use\\|finwright\\)\\_>" 1 font-lock-keyword-face)
    ("\\_<\\([a-z_]+\\)\\_>\\(?:\\s-+\\(?:\\(\\(?:\\sw\\|\\s_\\)+\\)\\|\"[^\"\n]*\"\\)\\)?\\s-*{"
     (1 font-lock-builtin-face)
     (2 font-lock-function-name-face nil t))
    ("\\_<\\([a-z_]+\\)\\s-*:" 1 font-lock-variable-name-face)
    ("\\_<[0-9]+\\(?:\\.[0-9]+\\)?\\s-*\\([°µ]?[A-Za-z]+[0-9]?\\(?:/[A-Za-z]+[0-9]?\\)*\\|%\\)"
     1 font-lock-type-face))
  "What gets a colour besides comments and strings.")

(defun finwright-indent-line ()
  "Indent the line by the number of blocks around it."
  (interactive)
  (let ((depth (save-excursion
                 (back-to-indentation)
                 (- (car (syntax-ppss)) (if (looking-at-p "[])}]") 1 0)))))
    (save-excursion (indent-line-to (* finwright-indent (max depth 0))))
    (when (< (current-column) (current-indentation))
      (back-to-indentation))))

;;;###autoload
(define-derived-mode finwright-mode prog-mode "Finwright"
  "Edit a hobby-rocket description."
  (setq-local comment-start "# "
              comment-start-skip "#+\\s-*"
              indent-line-function #'finwright-indent-line
              font-lock-defaults '(finwright-font-lock-keywords)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.finw\\'" . finwright-mode))

;;;###autoload
(define-derived-mode finwright-settings-mode conf-toml-mode "Finwright settings"
  "Edit the finwright.toml beside some designs.")

;;;###autoload
(add-to-list 'auto-mode-alist '("/finwright\\.toml\\'" . finwright-settings-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs
               (cons '(finwright-mode finwright-settings-mode) (lambda (&rest _) finwright-command))))

(provide 'finwright-mode)
;;; finwright-mode.el ends here
