;;; A session in a real Emacs: open, look, read, mend.  What was seen goes to a file as JSON.  -*- lexical-binding: t; -*-

(require 'package)
(package-initialize)
(require 'eglot)
(require 'flymake)
(require 'json)
(load (expand-file-name "editors/emacs/finwright-mode.el" (getenv "HOME_OF_FINWRIGHT")) nil t)
(setq finwright-command (list (getenv "FINWRIGHT") "lsp")
      eglot-confirm-server-initiated-edits nil
      make-backup-files nil)

(defvar seen nil "What was seen, by name.")

(defun note (name value) (push (cons name value) seen))

(defun wait (what condition)
  "Wait until CONDITION gives something, and give that."
  (let ((end (+ (float-time) 10)) value)
    (while (and (not (setq value (funcall condition))) (< (float-time) end))
      (accept-process-output nil 0.02))
    (or value (error "Nothing came of it: %s" what))))

(defun unknown-names ()
  "The findings on the misspelt name."
  (flymake-start)
  (seq-filter (lambda (one) (string-match-p "calber" (flymake-diagnostic-text one)))
              (flymake-diagnostics)))

(defun under (one)
  (buffer-substring-no-properties (flymake-diagnostic-beg one) (flymake-diagnostic-end one)))

(defun face-of (words)
  "The face at the first place where WORDS stand."
  ;; A batch has no display, so the colours have to be asked for.
  (font-lock-set-defaults)
  (font-lock-fontify-region (point-min) (point-max))
  (goto-char (point-min))
  (search-forward words)
  (format "%s" (get-text-property (match-beginning 0) 'face)))

(defun session ()
  (find-file (getenv "DESIGN"))
  (note 'mode (symbol-name major-mode))
  (note 'faces (mapcar #'face-of '("# language" "design \"" "outer" "mm\n" "\"Reed" "let " "body {")))
  (let ((text (buffer-string)))
    (indent-region (point-min) (point-max))
    (note 'indented (if (equal text (buffer-string)) "as it was" (buffer-string)))
    (set-buffer-modified-p nil))
  (call-interactively #'eglot)
  (let ((found (wait "the finding" #'unknown-names)))
    (note 'found (vconcat (mapcar #'under found)))
    (note 'message (flymake-diagnostic-text (car found))))
  (goto-char (point-min))
  (search-forward "lug front")
  (backward-char 2)
  (let ((hover (jsonrpc-request (eglot-current-server) :textDocument/hover
                                (eglot--TextDocumentPositionParams))))
    (note 'hover (plist-get (plist-get hover :contents) :value)))
  (goto-char (point-min))
  (search-forward "calber")
  (eglot-code-actions (match-beginning 0) (match-end 0) "quickfix" t)
  (wait "the fix" (lambda () (save-excursion
                               (goto-char (point-min))
                               (not (search-forward "calber" nil t)))))
  ;; An idle timer does this, and in a batch nothing is ever idle.
  (eglot--signal-textDocument/didChange)
  (wait "the end of the finding" (lambda () (null (unknown-names))))
  (note 'text (buffer-substring-no-properties (point-min) (point-max)))
  (eglot-shutdown (eglot-current-server))
  (find-file (expand-file-name "finwright.toml" (file-name-directory (getenv "DESIGN"))))
  (note 'settings-mode (symbol-name major-mode))
  (call-interactively #'eglot)
  (let ((found (wait "the settings' finding" (lambda () (flymake-start) (flymake-diagnostics)))))
    (note 'settings (flymake-diagnostic-text (car found))))
  (eglot-shutdown (eglot-current-server)))

(condition-case trouble
    (session)
  (error (note 'trouble (error-message-string trouble))))
(with-temp-file (getenv "SEEN")
  (insert (json-encode seen)))
