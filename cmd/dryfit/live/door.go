package live

import (
	"crypto/rand"
	"crypto/subtle"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"slices"
	"strings"
	"time"

	"dryfit/render/live"
)

// Door decides who is let in.
type Door struct {
	port  string
	hosts []string // names and addresses the page may be called by
	token string   // "" on loopback
}

// NewDoor returns the door of a listener. Where others than this machine can reach it, whoever
// comes needs a token, made anew each time.
func NewDoor(at net.Addr, named string) *Door {
	address, _ := netip.ParseAddrPort(at.String())
	d := &Door{port: portOf(at)}
	d.hosts = []string{"localhost", "127.0.0.1", "::1"}
	if address.Addr().Unmap().IsLoopback() {
		d.hosts = append(d.hosts, address.Addr().Unmap().String())
		return d
	}
	d.token = rand.Text()
	d.hosts = append(d.hosts, Addresses()...)
	if host, _, err := net.SplitHostPort(named); err == nil && host != "" {
		d.hosts = append(d.hosts, strings.ToLower(host))
	} else if named != "" {
		d.hosts = append(d.hosts, strings.ToLower(named))
	}
	if name, err := os.Hostname(); err == nil && name != "" {
		d.hosts = append(d.hosts, strings.ToLower(name), strings.ToLower(name)+".local")
	}
	return d
}

func portOf(at net.Addr) string {
	_, port, _ := net.SplitHostPort(at.String())
	return port
}

// Addresses lists the addresses of this machine that others can reach it by.
func Addresses() []string {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var out []string
	for _, a := range all {
		prefix, err := netip.ParsePrefix(a.String())
		if err != nil {
			continue
		}
		if ip := prefix.Addr().Unmap(); ip.IsGlobalUnicast() {
			out = append(out, ip.String())
		}
	}
	slices.SortStableFunc(out, func(a, b string) int { // four numbers first: they are the ones people type
		return strings.Count(a, ":") - strings.Count(b, ":")
	})
	return out
}

// Private reports whether only this machine can reach the page.
func (d *Door) Private() bool { return d.token == "" }

// Links returns the links to print: one, or one for each address others can use.
func (d *Door) Links(at net.Addr) []string {
	address, err := netip.ParseAddrPort(at.String())
	hosts := []string{"127.0.0.1"}
	if err == nil && !address.Addr().Unmap().IsUnspecified() {
		hosts = []string{address.Addr().Unmap().String()}
	} else if err == nil {
		if all := Addresses(); len(all) > 0 {
			hosts = all
		}
	}
	var out []string
	for _, h := range hosts {
		link := "http://" + net.JoinHostPort(h, d.port) + "/"
		if d.token != "" {
			link += "?token=" + d.token
		}
		out = append(out, link)
	}
	return out
}

// cookieName is under what the token is kept once the link was followed. A browser keeps one jar
// for all ports of a host: each has its name.
func (d *Door) cookieName() string { return "dryfit-token-" + d.port }

// guard lets in whoever calls the page by its own name, from itself, with the token where one
// is asked for; and says of every answer what a browser may do with it.
func (d *Door) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(answerTime)) // of refusals too; one that is worked out sets its own
		h := w.Header()
		h.Set("Content-Security-Policy", live.Policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		switch {
		case !d.host(r.Host):
			http.Error(w, "this page is not called by that name", http.StatusMisdirectedRequest)
		case !d.origin(r):
			http.Error(w, "this page answers to itself alone", http.StatusForbidden)
		case d.token == "":
			next.ServeHTTP(w, r)
		case r.Method == http.MethodGet && r.URL.Path == "/" && d.knows(r.URL.Query().Get("token")):
			http.SetCookie(w, &http.Cookie{Name: d.cookieName(), Value: d.token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode}) //nolint:gosec // there is no TLS on a local network
			http.Redirect(w, r, "/", http.StatusSeeOther)
		case d.cookie(r):
			next.ServeHTTP(w, r)
		default:
			http.Error(w, "open the link that dryfit printed: its token is missing", http.StatusUnauthorized)
		}
	})
}

// host reports whether a request names one of the page's own hosts and its port.
func (d *Door) host(named string) bool {
	host, port, err := net.SplitHostPort(named)
	if err != nil {
		host, port = named, "80"
	}
	return port == d.port && slices.Contains(d.hosts, strings.ToLower(strings.Trim(host, "[]")))
}

// origin reports whether a request comes from the page itself. One that changes something must
// say so; one that only reads may come from the address bar.
func (d *Door) origin(r *http.Request) bool {
	reads := r.Method == http.MethodGet || r.Method == http.MethodHead
	if o := r.Header.Get("Origin"); o != "" {
		u, err := url.Parse(o)
		return err == nil && u.Scheme == "http" && u.Host == r.Host
	}
	switch r.Header.Get("Sec-Fetch-Site") {
	case "same-origin":
		return true
	case "none", "":
		return reads
	}
	return reads && r.URL.Path == "/" && r.Header.Get("Sec-Fetch-Mode") == "navigate" // a link followed
}

func (d *Door) cookie(r *http.Request) bool {
	c, err := r.Cookie(d.cookieName())
	return err == nil && d.knows(c.Value)
}

func (d *Door) knows(token string) bool {
	return subtle.ConstantTimeCompare([]byte(token), []byte(d.token)) == 1
}
