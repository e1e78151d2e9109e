\version "2.24.0"
%% A LilyPond that stays: it has read the head and made a picture, and engraves each document in a fork of itself.
%%
%% in      FOLDER <tab> SECONDS     engrave FOLDER/body.ly there, within so many seconds; what else it reads meanwhile
%%                                  ends that fork
%% out     ready, once; then for each request: ok | failed | signal N | given-up
%%
%% It ends with its input. `filter` beside it is a system call filter, which each fork takes upon itself before it reads
%% its document: this process itself must fork.
#(use-modules (ice-9 rdelim) (ice-9 binary-ports) (rnrs bytevectors) (system foreign))

#(define (gs:engrave text)
   (let ((parser (ly:parser-clone)))
     (ly:parser-parse-string parser text)
     (not (ly:parser-has-error? parser))))

#(define gs:prctl
   (pointer->procedure int (dynamic-func "prctl" (dynamic-link))
                       (list int unsigned-long unsigned-long unsigned-long unsigned-long)))
#(define (gs:process-control! option . rest)
   (if (not (zero? (apply gs:prctl option rest))) (error "no process control" option)))

%% No process of the same user may look into this one, nor write to it or to its pipes; its forks neither.
#(gs:process-control! 4 0 0 0 0)  % PR_SET_DUMPABLE

#(define gs:filter (call-with-input-file "filter" get-bytevector-all #:binary #t))
#(define (gs:forbid!)
   (if (bytevector? gs:filter)
       (let ((program (make-bytevector 16 0)))  ; struct sock_fprog: the number of instructions, and where they are
         (bytevector-u16-native-set! program 0 (quotient (bytevector-length gs:filter) 8))
         (bytevector-u64-native-set! program 8 (pointer-address (bytevector->pointer gs:filter)))
         (gs:process-control! 38 1 0 0 0)  ; PR_SET_NO_NEW_PRIVS
         (gs:process-control! 22 2 (pointer-address (bytevector->pointer program)) 0 0))))  ; PR_SET_SECCOMP

%% A short document is made before collecting would free anything: collecting only copies what both have in common.
#(define gs:short 20000)
#(define (gs:fork folder seconds life)
   "In the fork: engrave what is in the folder, and end."
   (let ((status
          (catch #t
            (lambda ()
              (let ((nothing (open-fdes "/dev/null" O_RDWR)))
                (dup2 nothing 0)
                (dup2 nothing 1)
                (close-fdes nothing))
              (close-fdes (fileno (car life)))
              (chdir folder)
              (setrlimit 'cpu seconds (1+ seconds))
              (alarm seconds)
              (gs:forbid!)
              (let ((text (ly:gulp-file-utf8 "body.ly")))
                (if (< (string-length text) gs:short) (gc-disable))
                (if (gs:engrave text) 0 1)))
            (lambda (key . rest)
              (print-exception (current-error-port) #f key rest)
              1))))
     (flush-all-ports)
     (primitive-_exit status)))

#(define (gs:say text) (display text) (newline) (force-output))

#(define (gs:serve-one folder seconds)
   (let* ((life (pipe))  ; closed at its far end when the fork is no more, however it ended
          (pid (primitive-fork)))
     (if (zero? pid) (gs:fork folder seconds life))
     (close-port (cdr life))
     (let* ((said (if (char-ready?) '() (car (select (list (current-input-port) (car life)) '() '()))))
            (over (memq (car life) said)))
       (if (not over) (kill pid SIGKILL))
       (let ((status (cdr (waitpid pid))))
         (close-port (car life))
         (gs:say (cond ((not over) "given-up")
                       ((eqv? 0 (status:exit-val status)) "ok")
                       ((status:exit-val status) "failed")
                       (else (format #f "signal ~a" (status:term-sig status)))))))))

#(define (gs:serve)
   (let ((line (read-line)))
     (if (not (eof-object? line))
         (let ((parts (string-split line #\tab)))
           (if (= 2 (length parts)) (gs:serve-one (car parts) (string->number (cadr parts))))
           (gs:serve)))))

%% A picture like most, so that fonts, their shapes and what writes files are there before the first request.
#(gs:engrave "\\book { \\bookOutputName \"first\" \\paper { \\gsSnippetPaper } \\markup \\gs-picture { \\score {
  \\new Staff { \\cadenzaOn g'2\\p d''4\\f ^\\markup \\italic \"half\" cis''8 _\\markup \\bold \"1\" } \\layout { \\gsPicture } } } }")
#(gc)
#(gs:say "ready")
#(gs:serve)
